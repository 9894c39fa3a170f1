#include "app/window.hpp"

#define GLFW_INCLUDE_NONE
#include <GL/gl.h>
#include <GLFW/glfw3.h>
#include <imgui.h>
#include <imgui_impl_glfw.h>
#include <imgui_impl_opengl3.h>

#include <cmath>
#include <ctime>
#include <filesystem>

#include "app/save_seen.hpp"
#include "app/scene.hpp"
#include "driver/touch_size.hpp"
#include "kit/canvas.hpp"
#include "simulator/simulator.hpp"

namespace podrate::ui {
namespace {

constexpr double kFrameS = 1.0 / 20.0;  // while playing
constexpr double kLiveS = 0.25;         // a live machine may fall silent without an event
constexpr double kIdleS = 3600.0;       // while paused: sleep until something happens
constexpr int kFramesAfterEvent = 3;    // Dear ImGui settles hover and release over two more frames
constexpr int kLeastWidth = 800;
constexpr int kLeastHeight = 480;

std::string last_error;

void on_error(int code, const char* words) {
    last_error = std::string(words) + " (GLFW " + std::to_string(code) + ")";
}

Key key_of_code(int code, int scancode) {
    switch (code) {
        case GLFW_KEY_SPACE: return Key::space;
        case GLFW_KEY_ENTER:
        case GLFW_KEY_KP_ENTER: return Key::enter;
        case GLFW_KEY_ESCAPE: return Key::escape;
        case GLFW_KEY_BACKSPACE: return Key::backspace;
        case GLFW_KEY_DELETE: return Key::remove;
        case GLFW_KEY_TAB: return Key::tab;
        case GLFW_KEY_LEFT: return Key::left;
        case GLFW_KEY_RIGHT: return Key::right;
        case GLFW_KEY_UP: return Key::up;
        case GLFW_KEY_DOWN: return Key::down;
        case GLFW_KEY_HOME: return Key::home;
        case GLFW_KEY_END: return Key::end;
        case GLFW_KEY_PAGE_UP: return Key::page_up;
        case GLFW_KEY_PAGE_DOWN: return Key::page_down;
        case GLFW_KEY_F1: return Key::f1;
        case GLFW_KEY_F2: return Key::f2;
        case GLFW_KEY_F3: return Key::f3;
        case GLFW_KEY_F4: return Key::f4;
        case GLFW_KEY_LEFT_SHIFT:
        case GLFW_KEY_RIGHT_SHIFT:
        case GLFW_KEY_LEFT_CONTROL:
        case GLFW_KEY_RIGHT_CONTROL:
        case GLFW_KEY_LEFT_ALT:
        case GLFW_KEY_RIGHT_ALT: return Key::modifier;
        default: break;
    }
    const char* name = glfwGetKeyName(code, scancode);
    return name != nullptr && name[1] == '\0' ? key_of(*name) : Key::other;
}

Session& session_of(GLFWwindow* window) {
    return *static_cast<Session*>(glfwGetWindowUserPointer(window));
}

void on_key(GLFWwindow* window, int code, int scancode, int pressed, int mods) {
    if (pressed == GLFW_RELEASE) return;
    session_of(window).press({key_of_code(code, scancode), (mods & GLFW_MOD_SHIFT) != 0,
                              (mods & GLFW_MOD_CONTROL) != 0, pressed == GLFW_REPEAT});
}

void on_character(GLFWwindow* window, unsigned character) {
    session_of(window).type(static_cast<char32_t>(character));
}

// A day's folder, or its day.toml.
void on_drop(GLFWwindow* window, int count, const char** paths) {
    if (count < 1) return;
    std::filesystem::path path(paths[0]);
    if (path.filename() == "day.toml") path = path.parent_path();
    session_of(window).open_other(path);
}

double px_per_mm_of_screen() {
    GLFWmonitor* monitor = glfwGetPrimaryMonitor();
    const GLFWvidmode* mode = monitor != nullptr ? glfwGetVideoMode(monitor) : nullptr;
    if (mode == nullptr) return 0.0;
    ScreenSize screen = {mode->width, mode->height, 0, 0};
    glfwGetMonitorPhysicalSize(monitor, &screen.width_mm, &screen.height_mm);
    return px_per_mm(screen);
}

double processor_s() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

// Owns GLFW, the window and Dear ImGui's context; undoes what it did.
class Screen {
  public:
    Screen() = default;
    ~Screen() {
        if (imgui_) {
            ImGui_ImplOpenGL3_Shutdown();
            ImGui_ImplGlfw_Shutdown();
            ImGui::DestroyContext();
        }
        if (window_ != nullptr) glfwDestroyWindow(window_);
        if (glfw_) glfwTerminate();
    }
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;

    bool open(Session& session, const WindowSize& size) {
        glfwSetErrorCallback(on_error);
        glfw_ = glfwInit() == GLFW_TRUE;
        if (!glfw_) return false;
        // 3.2 draws more than 65,536 corners in one go, as a stack of charts needs.
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 2);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        window_ = glfwCreateWindow(size.width_px, size.height_px, "Podrate", nullptr, nullptr);
        if (window_ == nullptr) return false;
        glfwSetWindowSizeLimits(window_, kLeastWidth, kLeastHeight, GLFW_DONT_CARE, GLFW_DONT_CARE);
        glfwMakeContextCurrent(window_);
        glfwSwapInterval(0);
        glfwSetWindowUserPointer(window_, &session);
        glfwSetKeyCallback(window_, on_key);
        glfwSetCharCallback(window_, on_character);
        glfwSetDropCallback(window_, on_drop);
        session.set_px_per_mm(px_per_mm_of_screen());
        IMGUI_CHECKVERSION();
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        ImGui_ImplGlfw_InitForOpenGL(window_, true);
        ImGui_ImplOpenGL3_Init("#version 150");
        imgui_ = true;
        return true;
    }

    // Returns the processor time that it took to build the frame, without drawing it; 0 where none was drawn.
    double draw(Session& session) {
        int width = 0;
        int height = 0;
        glfwGetFramebufferSize(window_, &width, &height);
        if (width == 0 || height == 0) return 0.0;
        fit_fonts(scene_unit(session, static_cast<float>(width), static_cast<float>(height)));
        ImGui_ImplOpenGL3_NewFrame();
        ImGui_ImplGlfw_NewFrame();
        session.refresh();
        const double begun_s = processor_s();
        ImGui::NewFrame();
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        draw_scene(session, fonts_, size.x, size.y, true);
        ImGui::Render();
        const double built_s = processor_s() - begun_s;
        glViewport(0, 0, width, height);
        const Rgb ground = session.palette().ground;
        glClearColor(static_cast<float>(ground.r) / 255.0F, static_cast<float>(ground.g) / 255.0F,
                     static_cast<float>(ground.b) / 255.0F, 1.0F);
        glClear(GL_COLOR_BUFFER_BIT);
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        glfwSwapBuffers(window_);
        const auto seen = [&] {
            return rasterise(*ImGui::GetDrawData(), *ImGui::GetIO().Fonts, width, height, ground);
        };
        const std::filesystem::path here = std::filesystem::current_path();
        if (session.has_day() && session.view() == View::day) save_seen(session.desk(), here, seen);
        if (session.has_day() && session.view() == View::bench) save_seen(session.bench(), here, seen);
        const std::string title = session.title();
        if (title != title_) glfwSetWindowTitle(window_, title.c_str());
        title_ = title;
        return built_s;
    }

    [[nodiscard]] WindowSize size() const {
        WindowSize size;
        glfwGetWindowSize(window_, &size.width_px, &size.height_px);
        return size;
    }

    // By its frame. A session that has something to ask first keeps it open.
    [[nodiscard]] bool closed(Session& session) {
        if (glfwWindowShouldClose(window_) != GLFW_TRUE) return false;
        if (session.may_close()) return true;
        glfwSetWindowShouldClose(window_, GLFW_FALSE);
        return false;
    }

  private:
    // Type is drawn at its own size: made anew when the window's unit changes.
    void fit_fonts(float unit) {
        if (std::abs(unit / built_unit_ - 1.0F) < 0.02F) return;
        built_unit_ = unit;
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        fonts_ = load_fonts(*ImGui::GetIO().Fonts, unit, font_candidates_regular(), font_candidates_bold());
        ImGui_ImplOpenGL3_CreateFontsTexture();
    }

    GLFWwindow* window_ = nullptr;
    bool glfw_ = false;
    bool imgui_ = false;
    Fonts fonts_;
    float built_unit_ = 1e-6F;
    std::string title_;
};

}  // namespace

bool run_window(Session& session, const std::filesystem::path& folder, WindowSize& size, FrameBook& book,
                std::string& why) {
    Screen screen;
    if (!screen.open(session, size)) {
        why = last_error.empty() ? "no window system" : last_error;
        return false;
    }
    session.set_wake([] { glfwPostEmptyEvent(); });
    if (!folder.empty()) session.open(folder);
    double last_s = glfwGetTime();
    double due_s = last_s;
    int frames_left = kFramesAfterEvent;
    while (!screen.closed(session) && !session.quit()) {
        const bool playing = session.playback().playing();
        const double now_s = glfwGetTime();
        if (!playing) session.playback().tick(0.0);
        if (playing) session.playback().tick(now_s - last_s);
        session.drive_on(now_s - last_s);
        last_s = now_s;
        const double build_s = screen.draw(session);
        book.add(build_s, glfwGetTime() - due_s, playing && session.playback().playing());
        if (session.has_day()) book.day_open();
        if (frames_left > 0) --frames_left;
        const bool drives = session.simulator() != nullptr && !session.simulator()->paused();
        if (session.playback().playing() || drives || frames_left > 0) {
            due_s = due_s + kFrameS > now_s ? due_s + kFrameS : now_s;
            const double wait_s = due_s - glfwGetTime();
            if (wait_s > 0.0) {
                glfwWaitEventsTimeout(wait_s);
            } else {
                glfwPollEvents();
            }
        } else {
            glfwWaitEventsTimeout(session.live() ? kLiveS : kIdleS);
            if (!session.live()) frames_left = kFramesAfterEvent;
            last_s = glfwGetTime();
        }
    }
    session.stop_opening();
    size = screen.size();
    return true;
}

}  // namespace podrate::ui
